"""Spanish frames for signs as other voices tell them (Mexico, Central and South America, the Caribbean, Spain, and
Spanish with English in it); the notation is that of frames_en. Idioms and everyday things stand below."""

from __future__ import annotations

from bot.understanding.context import table, words_of

CLASSES = """
COMIDA = suadero pupusa brisket marraqueta lomo mofongo ciruela pulpo anticucho cuy calamar chinchulin cacahuate
    asada bolillo gandules gallopinto camaron palta aguacate bocadillo pan_de_bono trocito presa tinto steak chicken
ATASCADO = trancado trancada atravezado atravesada plantado planto encajada frenada frenado stuck detenida trabo
    hizo_tapon
BAJA = cede ceder quita_ni baja_ni se_va avanza
NOPUEDO = no_logro no_logra no_consigue incapaz_de no_hay_forma no_hay_manera no_alcanza no_puedo_ni no_podia no_pudo
    no_puede_ni
TRAGAR = swallow tragarmela pasarla pasarlas pasarsela deglutir tragarse
SALIVA = escupitajo babita babitas saliva_que spit
BABEA = babeaba chorreando chorrea mojado_de_baba empapada_de_baba
ESCUPE = botarla botando botar soltarla tirarla echarla
VASO = maceta bacinica cubeta cup lavaplatos trapo balde papel_de_cocina
VOMITA = arquee arqueo threw_up vomitted bomito bomite devolvio vomitaba trasboco compuso
HECES = popo obrando obro obre hice_del_cuerpo deposiciones excremento excrementos hago_del_cuerpo
ROJO = vino rojiza dark color_vino
ALQUITRAN = melenica melenicas melena petroleo chapopote alquitran regaliz brea aceite_quemado
AHOGO = boqueando boqueo asfixiada asfixiado sin_resuello no_agarra_aire no_coge_aire me_ahogo_estando falta_resuello
RESPIRA = resuello inspiro inspira inhalada inhalo inhala respiradero inspirar
RESPMALA = roncosa rasposa pitido pitidos chiflando chiflido silbo silba chirrido raspa aspero
CARA = lenguita labiecito labiecitos carita cachetitos parpados trompa jeta bemba cachetes parpado pomulos cuello
    cogote uvula glotis papada lips boquita
HINCHA = hinchazon cuelga_del hinchadito hinchadita swollen edematosa inflada inflado hinchazon gorda gordo
    grandota engordando ancho abultando abultado
    hinchandose crecieron crecio creciendo gruesa del_tamaño globo
RONCHAS = hives comezon_y_rojas
PECHO = precordial pechito corazon costillar esternon torax pecho
DOLOR = opresion apretado aplastandome estruja prensando tenaza punalada pesa colico congoja
FUERTE = bestial brutal brutales bestia aplastandome tenaza nunca_habia_llorado 9_de_10 10_de_10 sudor_frio
    me_dobla grite encorvado enorme partirme me_parte atraviesa
COLAPSO = patatus_feo disparates balbucea borracho desorientada inconciente se_le_doblaron no_responde tirado_al_lado
    perdio_el_sentido se_desplomo desvanecio
FIEBRE = hervor fever fiebrecita afiebrado calenton volando_en_fiebre
MATARSE = estorbar no_va_a_estorbar tirarme_al colgar_se se_va_a_colgar me_voy_a_colgar despidiendose
    better_off_sin ya_tengo_pensado_como tengo_el_frasco_en_la_mano
EMBARAZO = dos_rayitas mama_en_camino espero_bebe
DEBIL = desguanzada desguanzado flojedad tired washed_out sin_pila
MAREO = se_me_nubla veo_lucecitas lucecitas nubla_la_vista
"""

FRAMES = """
impaction_now : COMIDA <8 ni_pa_lante|ni_sube|ni_arriba|no_cede|hizo_tapon|planto|frenada ! LEJOS
impaction_now : COMIDA <6 me <1 hizo tapon
impaction_now : sigue|todavia <2 lo|la tengo ahi
impaction_now : trago|tragado <6 ficha|moneda|bolita|pila|juguete|hueso
impaction_now : ni pa|para <2 lante|adelante|arriba <3 atras|abajo
cannot_swallow_saliva : NOPUEDO|no <3 TRAGAR <5 SALIVA|spit|babas|liquido|liquidos|agua|gota
cannot_swallow_saliva : SALIVA|baba|babas <10 NOPUEDO|no|sin <4 TRAGAR|pasarla|pasarlas|irse|baje
cannot_swallow_saliva : empapada|mojado|mojada|empapado|chorreando|charquitos <5 baba|saliva|menton|barbilla
cannot_swallow_saliva : se le|me <2 chorrea|cae <3 baba|saliva ! nieto nieta bebe_hermoso
cannot_swallow_saliva : rollo|pañuelo|cubeta|bolsa|toalla <8 saliva|babas|escupitajo|baba
cannot_swallow_saliva : agua|liquido|liquidos|bebida|manzanilla|suero|todo <3 afuera ! jugar trabajo
cannot_swallow_saliva : no|sin|incapaz <4 beber|tragar <4 gota|agua|sorbito|nada|gelatina
cannot_swallow_saliva : no <2 le|me <1 entra|entran|pasa|bajan <3 liquido|liquidos|agua
cannot_swallow_saliva : ni <3 sorbito|gota|sorbo
cannot_swallow_saliva : los liquidos <2 rebotan|devuelvo
bleeding : VOMITA <8 SANGRE|roja|ROJO|blood ! NOSANGRE jugo
bleeding : SANGRE|blood <6 VOMITA|botas|sudadera|bacinica ! NOSANGRE dedo
bleeding : HECES <6 negro|negra|negras|ALQUITRAN|petroleo
bleeding : obrando|obro|hice_del_cuerpo <4 negro|petroleo|ALQUITRAN
bleeding : deposicion|deposiciones <2 ALQUITRAN
bleeding : trapo|piso <3 quedo color vino|sangre
breathing_trouble : estridor ! sin no
breathing_trouble : RESPMALA|pitido|chiflando|silbo <8 RESPIRA|aire|garganta ! perro tetera
breathing_trouble : RESPIRA|respiracion|inspira <6 RESPMALA
breathing_trouble : resuello|aire <3 no <2 alcanza|entra
breathing_trouble : no <3 llenar|llena <2 pulmones
breathing_trouble : oximetro|saturacion <4 78|79|80|81|82|83|84|85|86|87|88|89|90
breathing_trouble : mete <3 barriga|panza|costillas <2 adentro|hacia|dentro
breathing_trouble : dedos|labios|labiecitos|labiecito|boquita|uñas <4
    violeta|violetas|violaceos|grises|azulitos|azules|morados|moradas|azuladas|moraditos ! moras uva helado
allergic_reaction +airway_swelling : CARA <8 HINCHA ! panza
allergic_reaction +airway_swelling : HINCHA <5 CARA ! panza gases barriga
allergic_reaction +airway_swelling : labio|labios|lengua|cara|boca|parpados|cachetes <6 como|tamaño <3
    globo|salchicha|salchichas|hot|pan|bolsas|guineo|pelota|masa|sapo
allergic_reaction +airway_swelling : creciendo|crecio <3 doble|labio|lengua|boca
chest_pain +severe : PECHO <6 FUERTE|brutal|sudor|brazo|mandibula|espalda ! voz
chest_pain +severe : PECHO <8 gris|palido|encorvado|enderezar|cemento|bulto|tabla
chest_pain +severe : estruja|aplasta|prensan|prensando|aprieta <4 corazon|pecho|esternon|adentro
chest_pain +severe : PECHO <6 mandibula|brazo|irradiada
chest_pain +severe : DOLOR <4 PECHO <8 mandibula|brazo|irradiada|sudor|nauseas
chest_pain : se agarra|toca <2 PECHO
chest_pain +severe : atravesado|atravezado|clavado <3 pecho|esternon <8 fuerte|aguanto|espalda
breathing_trouble : respira|respiro|respirando <2 cortito|corto|agitado|rapidito ! despues correr
bleeding : HECES|deposicion <5 brea|petroleo|melena
+taken_twice : mg <3 en_vez_de <2 1|2|uno|dos|medio
+child_took_it : primito|hermanito|hermanita|nieto|nieta|sobrinito|vecinito|sobrina|sobrino <8
    bebio|bebido|bebio_de|trago|tomo <4
    vaso|vasito|frasco|medicina|golpe|preparado|ampolla
chest_pain +severe : elefante|losa|cincho|piedra <6 PECHO
chest_pain : colico|punzada|puñalada|opresion|tenaza <6 PECHO
adrenal_sign +collapse : no <4 despertar|despierta|despertarla|despertarlo|reacciona|responde ! alarma correo mensaje
adrenal_sign +collapse : no <1 sabe|se <2 que|donde|onde <2 dia|esta|stoy|estoy|año ! cita farmacia entrega
adrenal_sign +collapse : no reconoce
adrenal_sign +collapse : solo|apenas <1 gime|gruñe|balbucea
adrenal_sign +collapse : super|muy|bien|todo <1 confundido|confundida|confused
adrenal_sign +collapse : me_fui|fui|cayo|cai <2 suelo|piso ! celular vaso
adrenal_sign +collapse : se me fue la luz ! casa barrio cuadra
adrenal_sign +collapse : brazos <3 caen
adrenal_sign : sal <4 cucharadas|mano|sandia|lamer
adrenal_sign : pantalones <3 caen
adrenal_sign : no|sin <2 crece|crecer|crecido ! pelo barba
adrenal_sign : baje|bajado|perdi|perdido <2 5|6|7|8|9|10|cinco|seis|siete <1 kilos|kg
self_harm : tirarme|tirarse|lanzarme|aventarme <4 tren|puente|paso|balcon|metro|azotea
self_harm : carta <3 despidiendose|despedida
self_harm : no <2 veo|encuentro <3 sentido|point|caso ! medicina mezcla
self_harm : better|mejor off? sin mi ! app casa
self_harm : me quemo|corto|corte|queme <6 cigarro|navaja|piernas|brazos|no_pensar
self_harm : hice daño ! rodilla tobillo jugando espalda
self_harm : daño <4 navaja|cuchillo|proposito
self_harm : dios me llevara|lleve
self_harm : regalando <3 cosas ! casa mudanza
self_harm : ya no <2 estorbar
self_harm : se_va|me_voy|voy|va <2 a? colgar|ahorcar ! ropa cuadro telefono
self_harm : tengo <2 frasco <3 mano
self_harm : no|no_es <2 vida|vivir <3 asi|comer
thrush : BOCA|tongue|lengua <6 capa|alfombra|algodon <2 blanca|gruesa
odynophagia : swallowing|tragar <2 hurts|duele|quema
odynophagia : rasguña|raspando|quema <4 bajando|tragar|bocado|dolor
odynophagia : bocado|trago <4 raspando|quema|arde|pincha
herpes_sign : fogazo|boqueras|cold_sore|ampollitas <6 boca|labio|labios|lip
herpes_sign : cold_sore|cold sore
fever : calientito|calientita|ardiendo <4 38|39|40|cuerpito
worse_dysphagia +marked_dysphagia : cada_vez|cada_dia <5 dificil|angosto|lento|peor ! RONCA voz
worse_dysphagia +marked_dysphagia : ahora|hasta <4 lento|hora|demora|empujon|papilla <8 agua|plato|bajar
worse_dysphagia +marked_dysphagia : me demoro|tardo <6 almorzando|comer|comiendo
worse_dysphagia +marked_dysphagia : pararse|pararme <3 mesa <4 bajara|baje|bajar
impaction_resolved : COMIDA <10, luego|despues|salio|terminando|termino|sali <2 bajo|yendose|paso|irse|bajando
impaction_resolved : COMIDA <10, empuje|vomite|saco|expulse <4 soda|agua|pedazo|listo|tosiendo
+taken_twice : dosis|tome|racion <12, otra|repetida <4 12|10|despues|vez|dos
+taken_twice : disparos|ampollas|inhalaciones|puffs|dosis <4 en_vez_de|cuando|y_eran|y_son|en_lugar_de <5
    una|uno|dos|un|1|2|tocaba|tocaban|debian|eran ! quedan
+taken_twice : tambien <2 le|me <1 dio|di|dieron <4 medicina|dosis|ampolla|jarabe|mezcla ! receta permiso
+taken_twice : le|me <1 dio|dieron <4 tambien|otra_vez|de_nuevo ! fiebre vomito tos hambre
adrenal_sign : cara <3 redonda|luna|hinchada_y_redonda <10, moretones|moreton|estrias|kilos|peso
adrenal_sign : no|sin|ni <3 crece|crecido ! pelo barba planta
+taken_twice : dos <1 veces|lotes ! al_dia semana
+child_took_it : NINO|prima|primo <8 inhalador|mezcla|vasito <6 disparos|trago|bebio|echo
allergic_reaction : rojas|granitos|brotao|brotado|habones <5 comezon|pica|rasca|torso|cuerpo
"""

IDIOMS = table("""
sangra_el_bolsillo sin_aliento_con sin_aliento_de_tanto sin_aliento_al_ver vuelco_el_corazon ni_se_me_pasa
estoy_atascada_en estoy_atascado_en atascada_en_el_trafico atascado_en_el_trafico calor_que_te_ahogas calor_que_ahoga
analisis_de_sangre examen_de_sangre examenes_de_sangre prueba_de_sangre pruebas_de_sangre muestra_de_sangre
tubos_de_sangre tipo_de_sangre banco_de_sangre done_sangre dono_sangre sacaron_sangre saca_sangre extraccion_de_sangre
calor_sofocante se_llevaron_el_susto
fiebre_del_mundial fiebre_de_sabado fiebre_del_futbol se_llama_fiebre me_ahogo_en_un_vaso ahogada_de_trabajo
ahogado_de_trabajo ahogada_en_trabajo ahogado_en_trabajo huevos_ahogados torta_ahogada calor_asfixiante
me_muero_de_risa muero_de_hambre muero_de_sueño muerto_de_risa muerta_de_risa muero_de_ganas muero_de_vergüenza
cae_la_baba_con se_me_cae_la_baba_con babeo_por sangre_falsa sangre_de_mentira casi_me_desmayo_al_ver
casi_me_desmayo_cuando_vi casi_me_da_un_infarto casi_me_da_un_patatus doble_turno doble_sueldo doble_jornada
nudo_de_emocion matar_de_un_infarto tragar_coraje trague_coraje se_me_hincha_de_orgullo ardio_la_cara_pero
sangre_nueva fiebre_amarilla cabeza_hueca chupar_sangre_los_zancudos me_sacaron_sangre sacar_sangre donar_sangre
corazon_roto nada_grave
""")

EVERYDAY = words_of("""
camion fregadero tractor taladro manguera semaforo ascensor celular telefono batidora licuadora impresora
computadora pagina cuestionario app cremallera maleta puerta coche carro
autobus autopista trafico tubo tuberia lavadora nevera refrigerador pila bateria inhalador boquilla tapa internet
sarten olla silla mesa techo carpa sofa horno licuado ventana reloj perra perro gato motor moto avion
""")

BODILY = words_of("""
garganta esofago pecho esternon cuello boca lengua labios cara estomago barriga tragar trago tragado saliva vomito
vomite vomitar heces popo respirar respiro aire comida bocado dolor duele sangre comi comer pedazo trozo costillas
""")

PLACED = words_of("en con a de por sobre junto tras desde al del bajo hacia contra")
