"""Spanish word classes of the frames (Spain and the Americas). Accents are removed before matching; `_` joins the
words of a phrase."""

CLASSES = """
COMIDA = comida cena almuerzo desayuno bocado bocados trozo trozos pedazo pedazos pedacito trocito cacho pollo carne
    res cerdo filete bistec bife chuleta cordero pavo jamon salchicha tocino hamburguesa pescado atun salmon camaron
    gambas pan tostada bocadillo sandwich torta pizza arroz pasta fideos espagueti papa papas patata patatas manzana
    uva uvas zanahoria platano banana naranja lechuga ensalada huevo huevos tortilla tortillas cereal avena nuez
    nueces cacahuete mani queso pastel galleta galletas palomitas maiz frijol frijoles taco tacos arepa pastilla
    pastillas capsula tableta comprimido hueso espina bolo fruta verdura verduras chorizo empanada croqueta milanesa
    alimento alimentos bolo_alimenticio solidos asado pupusa tamal burrito elote melocoton durazno pera semilla
    pellejo piel_de
COSA = algo esto eso todo
ATASCADO = atascado atascada atascados atrapado atrapada atorado atorada atorados trabado trabada trancado trancada
    atravesado atravesada pegado pegada parado parada tapado tapada bloqueado bloqueada obstruido obstruida
    atragantado atragantada encajado encajada clavado clavada incrustado detenido detenida alojado estancado
    estancada enganchado enganchada atracado atracada atollado atoro atora atasco atasca trabo traba atranco atranca
    tranco atraganto atraganta atascar atorar atragante atorando atascando atragantando atragantar atraviesa
    atraveso atore atasque trabando me_quedo_ahi quedo_ahi se_quedo_en se_me_quedo_en
PUESTO = garganta esofago pecho esternon cuello gaznate tragadero medio_camino mitad buche
LEJOS = autopista carretera sarten fila cola obra trafico atasco_de_trafico puerta coche carro auto metro bus tren
    ascensor elevador trabajo oficina reunion
    telefono celular movil app tapa tapon botella frasco ampolla_atascada impresora llave cremallera cierre internet
    wifi nariz oido nieve cajon aplicacion tarjeta paquete correo envase cinturon fregadero vaso cuchara persiana
    lavabo tuberia inhalador boquilla maleta
NOV = no ni tampoco nunca apenas
BAJA = baja bajan bajo bajar bajado bajaba pasa pasan paso pasar pasado pasaba mueve mueven movido moverse entra
    entran entrar avanza sube_ni_baja sube resbala quiere_bajar quiere_pasar deja_pasar termina_de_bajar
    acaba_de_bajar acaba_de_pasar termina_de_pasar ha_bajado ha_pasado
NADA = nada ni_el_agua ni_agua ni_liquidos ni_siquiera_agua
NOPUEDO = no_puedo no_consigo no_logro no_soy_capaz_de no_podia no_puede apenas_puedo casi_no_puedo no_alcanzo
    no_me_deja no_pude no_he_podido imposible ya_no_puedo no_logra no_consigue casi_no
TRAGAR = tragar trago pasar tragarme tragarlo tragarla deglutir tragando trague ingerir
LIQUIDO = agua liquido liquidos bebida refresco jugo zumo leche cafe te caldo sopa
VUELVE = rebota me_rebota lo_echo rebotan vuelve_a_subir se_me_devuelve se_devuelve devuelvo regresa vuelve
    sube_otra_vez se_regresa se_me_regresa lo_devuelvo la_devuelvo vuelve_para_arriba sale_otra_vez se_me_sube
    vuelve_arriba regurgito lo_regreso se_viene_para_arriba me_viene_para_arriba vuelve_a_salir
SALIVA = saliva baba babas salivas espuma espumarajo
BABEA = babeo babeando babear babea salivando
ESCUPE = escupir escupo escupiendo escupe escupiendola echar
VASO = vaso taza cubo bolsa palangana cubeta lavabo panuelo servilleta balde tarro
SANGRE = sangre sangrado sangro sangrando sangra coagulos coagulo sangriento ensangrentado sanguinolento hemorragia
ROJO = rojo roja rojos rojizo negro negra negros negras oscuro oscura marron cafe_oscuro granate
VOMITA = vomito vomite vomitar vomitando vomita vomitado vomitos devolvi devolver devuelvo devolviendo arcadas
    guacareo guacare arroje arrojando arrojar tosiendo toso tosi tos trasboque trasbocar vomitada buitre
VOMITO = vomito vomite vomitar vomitando vomita vomitado vomitos devolvi devolviendo arrojando arroje guacare
    trasboque arcadas
HECES = baño heces caca popo deposicion deposiciones excremento excrementos mierda evacuacion evacuaciones cagar
    cague bano inodoro retrete ano papel_higienico defecar defeque hacer_del_bano materia_fecal hago_caca diarrea
ALQUITRAN = alquitran brea chapopote petroleo pegajosa pegajosas
POSOS = posos_de_cafe pozos_de_cafe cafe_molido borra_de_cafe asientos_de_cafe granos_de_cafe posos concho_de_cafe
NOSANGRE = analisis analitica presion_de_sangre dedo nariz encias regla donar done rodilla prueba_de_sangre afeitar
    azucar_en_sangre naranja_sanguina menstruacion examen_de_sangre
RESPIRA = respirar respiro respiracion respira respirando aire aliento
CUESTA = cuesta dificultad dificil problemas trabajo dificultades cansa
RESPMALA = mal rapido ruidosa ruidoso pitos silbidos agitada dificil fatal pesado corta agitado entrecortada
    superficial
AHOGO = falta_el_oxigeno no_agarro_aire no_jalo_aire me_ahogo me_asfixio ahogando asfixiando asfixia ahogo asfixio
    falta_de_aire falta_el_aire falta_aire sin_aire sin_aliento sibilancias me_estoy_ahogando ahogandome
    pitidos_en_el_pecho silbidos_en_el_pecho disnea me_falta_el_aire no_me_entra_el_aire no_me_entra_aire
    no_entra_aire crisis_de_asma me_quedo_sin_aire
CARA = cara labio labios lengua garganta boca ojo ojos parpados rostro campanilla
HINCHA = globos globo enormes agrandada agrandados hincha hinchan hinchado hinchada hinchados hinchadas hinchando
    hincho hincharon inflama inflamo inflamado inflamada inflamando inflamados inflamaron hinchazon enorme
    inflamadas hincharse cerrando cierra cerrado
RONCHAS = ronchas roncha sarpullido urticaria erupcion habones salpullido granitos alergia alergica rash
    picazon_por_todo picor_por_todo me_pica_todo_el_cuerpo reaccion_alergica
ANAFIL = anafilaxia anafilactico anafilactica angioedema shock_anafilactico choque_anafilactico
PECHO = pecho esternon torax costillas
DOLOR = dolor dolores duele duelen dolia doler dolio dolorido presion opresion molestia molestias punzada punzadas
    pinchazo pinchazos ardor arde quema apretado aprieta oprime pesadez peso tirantez calambre
FUERTE = fuerte fuertes fuertisimo horrible insoportable agudo aguda intenso intensa terrible severo severa
    muchisimo repente subito subita desgarrador peor_dolor espalda muy_mal brutal atroz insufrible mortal punzante
    repentino repentina tremendo me_mata mandibula brazo_izquierdo grave
FIEBRE = fiebre calentura febril escalofrios tiritando tiritona temperatura_alta fiebron destemplado destemplada
    fiebres ardiendo_en_fiebre tengo_temperatura con_temperatura tiritera escalofrio mucha_temperatura sudores_frios
    hirviendo ardiendo_de_fiebre tiene_temperatura
NOFIEBRE = calle afuera sol horno playa clima labio labios boca lengua
HERPES = herpes calentura_en_el_labio calentura_en_la_boca calenturas_en fuegos fuego_en afta aftas
    ulceras_en_la_boca boquera boqueras_no pupa_en_el_labio herpes_labial llagas_en_la_boca calentura_labial
    ulcera_bucal ulceras_bucales fuego_labial postillas culebrilla fogaje
AMPOLLA_BOCA = ampollas ampollitas llaga llagas ulcera ulceras vejigas vesiculas heridas pupas pupa costra costras
    calentura calenturas fuego fuegos herida
BOCA = boca labio labios lengua encia encias mejilla mejillas cachetes paladar garganta amigdalas carrillos cachete
    lenguita boquita
BLANCO = blanco blanca blancos blancas blanquecino blanquecina blanquecinas blanquecinos blancuzco blancuzca
    blanquito blanquita blanquitos blanquitas nata lechosa lechoso cremosa blanquesino
MANCHA = mancha manchas manchitas manchita placa placas capa puntos puntitos parche parches cosa cosas algo pelusa
    bolitas costra grumos pasta_en pelicula natas granitos cosillas lunares manchones plaquitas
CANDIDA = candida candidiasis hongo hongos muguet algodoncillo sapo_en_la_boca moniliasis candidosis micosis
    requeson
NOBLANCO = vino arroz pan camisa pared hoja chocolate polvo dientes ropa piel brazo azucar cafe leche papel
SABOR = algodon no_noto_el_sabor sabor_metalico sabor_a_metal perdi_el_gusto sin_gusto no_me_sabe no_saboreo
    perdido_el_gusto no_siento_el_sabor no_siento_sabores sabe_a_metal no_noto_sabor no_le_siento_sabor
    perdi_el_sabor
COMISURA = comisuras comisura boqueras boquera
GRIETA = agrietadas agrietada rojas roja grietas rajadas partidas irritadas inflamadas abiertas duelen cortadas
DUELE = duele duelen dolor dolores dolia doloroso dolorosa arde ardor ardia quema quemazon quemando escuece pica
    lastima raspa cuchillos cuchillas cristales vidrios vidrio clavos mata molesta irrita hace_dano fatal_dolor
    pinchos agujas cuchillo ardiendo quemada dolio lija
TRAGANDO = tragar trago al_tragar cuando_trago pasar_la_comida paso_la_comida pasar_comida comer como beber bebo
    pasar_saliva trague tragando cuando_como comiendo al_comer al_beber pasar_agua pasar_alimentos baja_la_comida
    pasa_la_comida bajar_la_comida
RONCA = ronca ronco ronquera afonica afonico afonia sin_voz disfonia voz_de_pito perdi_la_voz carraspera voz_tomada
    perdido_la_voz
VOZMALA = tomada ronca rasposa se_me_va quebrada rara apagada cambiada se_fue no_me_sale grave aspera gastada
    cascada debil fea perdida carrasposa
MAREO = mareado mareada mareo mareos mareo_mucho vertigo vertigos se_me_va_la_cabeza da_vueltas aturdido aturdida
    atontado atontada me_mareo desvanecimiento flojera_en_las_piernas vahido vahidos mareando
DEBIL = debil debilidad sin_fuerzas sin_energia sin_fuerza agotado agotada agotamiento muy_cansado muy_cansada
    cansancio fatiga fatigado fatigada decaido decaida sin_ganas_de_nada cansada_siempre cansado_siempre hecho_polvo
    hecha_polvo flojera temblores no_puedo_con_mi_alma tan_cansada tan_cansado desfallecido sin_animo rendido_todo
    super_cansado super_cansada
CANSADO = cansado cansada
ADREXTRA_ES = nauseas nausea sin_apetito sin_hambre bajando_de_peso perdido_peso perdiendo_peso no_tengo_hambre
    dolores_musculares mareado mareada levantarme ganas_de_vomitar
COLAPSO = me_fui_al_piso me_fui_al_suelo cai_al_piso cai_al_suelo desvanecida no_me_sostengo desplome desplomo
    desmaye desmayo desmayado desmayada desmayando desmayarme perdi_el_conocimiento perdio_el_conocimiento
    cai_redondo cai_redonda inconsciente confundido confundida confusion desorientado desorientada no_reacciona
    no_despierta convulsion convulsiones colapso colapse se_desmayo no_responde me_desplome desvaneci se_desvanecio
NOCOLAPSO = confundido_con dosis_es cual instrucciones horario hora_de
MATARSE = sentido_a_vivir sentido_a_seguir_viviendo no_quiero_seguir no_le_veo_sentido_a_la_vida matarme suicidarme
    suicidio suicidar quitarme_la_vida no_quiero_vivir quiero_morir me_quiero_morir quiero_morirme
    no_quiero_seguir_viviendo acabar_con_mi_vida acabar_con_todo hacerme_dano no_quiero_estar_aqui mejor_muerto
    mejor_muerta cortarme_las_venas ojala_estuviera_muerto ojala_estuviera_muerta autolesion ganas_de_morir
    no_vale_la_pena_vivir terminar_con_todo desaparecer_para_siempre estarian_mejor_sin_mi no_quiero_despertar
    lastimarme dejar_de_vivir sin_ganas_de_vivir sobredosis mejor_sin_mi no_tengo_ganas_de_vivir
    terminar_con_mi_vida quiero_desaparecer ya_no_quiero_vivir
EMBARAZO = prueba_positiva salio_positiva prueba_salio_positiva test_positivo embarazada embarazo espero_un_bebe
    esperando_un_bebe retraso_menstrual prueba_de_embarazo no_me_baja_la_regla no_me_ha_bajado_la_regla
    quedar_embarazada encinta buscando_un_bebe lactancia dando_el_pecho esperamos_un_bebe no_me_ha_bajado_el_periodo
    quede_embarazada preñada tengo_un_retraso dando_pecho esperando_bebe voy_a_tener_un_bebe amamantando
OLVIDO = olvide olvido olvidado olvidaron olvidando salte saltado saltada perdi_la_dosis pase_la_dosis
DOSISOBJ = dosis anoche tomarla tomarlo tomar ayer hoy noche mañana medicina medicamento medicacion inhalador puffs
    ampolla tarde jarabe dias dos tres una otra_vez
NOTOME = no_la_tome no_lo_tome no_me_la_tome no_la_he_tomado no_lo_he_tomado no_he_tomado no_tome no_me_lo_tome
    no_me_tome no_la_tomo no_me_la_he_tomado llevo_dias_sin_tomarla sin_tomarla sin_tomarlo
NOOLVIDO = agitar agitarlo mezclar mezclarlo enjuagar enjuagarme cita decir preguntar cumpleaños contraseña
    contestar avisar responder
ACABO = se_me_acabaron se_me_acabo se_me_acabaron_las me_quede_sin_ampollas me_quede_sin_medicina
    me_quede_sin_medicamento no_tengo_ampollas no_me_quedan sin_ampollas
DORMIDO = quede_dormido quede_dormida dormi_antes
DEJAR = dejar_el_tratamiento dejar_de_tomar deje_de_tomar deje_de_tomarla deje_de_tomarlo quiero_dejar quiero_parar
    parar_el ya_no_quiero_tomar no_quiero_tomar no_quiero_seguir no_quiero_mas lo_deje la_deje he_dejado_de dejarlo
    dejarla ya_no_la_tomo ya_no_lo_tomo no_quiero_continuar suspender abandonar ya_no_quiero_tomarlo
    ya_no_quiero_tomarla parar_con harto_de_este harta_de_este dejar_la_medicina dejar_el_medicamento deje_el
    dejarme_de_tomar ya_no_quiero_seguir harta_de_tomar harto_de_tomar
RECETO = recetaron receto dieron dio tomando tomo empece empezado puso pusieron mandaron mando recetado
FARMACO = antibiotico antibioticos claritromicina eritromicina azitromicina amoxicilina itraconazol ketoconazol
    fluconazol voriconazol posaconazol ritonavir cobicistat prednisona prednisolona dexametasona diltiazem
    verapamilo ciclosporina carbamazepina rifampicina nistatina antidepresivo antidepresivos corticoides antifungico
    penicilina aciclovir hierba_de_san_juan antivirales antiviral
MEDNUEVO = medicamento_nuevo medicina_nueva pastillas_nuevas otro_medicamento otra_medicina tratamiento_nuevo
    nuevo_medicamento nueva_medicina nuevas_pastillas inhalador_nuevo nuevo_inhalador pastilla_nueva
MEJOR = mejor mejora mejorado mejorando mejore facil fenomenal genial estupendamente normal sin_problema
    sin_problemas de_maravilla como_de_todo
MEJORCON = trago tragar como comer estoy mucho siento comida paso bastante voy puedo mas encuentro va de_todo
PEOR = batallo batallando peor peores cuesta cuestan dificil dificultad lento lenta despacio trabajo problemas
    empeorado empeorando mas_lento mal
DISF = tragar trago comer comida solidos carne pan tragando alimentos deglutir
DISFAGIA = disfagia dificultad_para_tragar problemas_para_tragar me_cuesta_tragar
SOLOLIQ = solo_paso_sopas nada_mas_paso_sopas nada_mas_sopas puras_sopas solo_liquidos solo_puedo_con_sopa solo_sopa
    solo_caldo puros_liquidos no_puedo_con_los_solidos no_puedo_comer_solidos no_puedo_con_solidos solo_pure
    solo_pures solo_puedo_tomar_liquidos puedo_con_sopa no_tolero_solidos solo_papillas solo_batidos
    solo_me_entra_liquido
NINO = hijo hija niño niña nene nena bebe hijos nieto nieta sobrino sobrina hermano hermana hermanito hermanita
    mujer marido esposo esposa perro gato chiquito chiquita peque
TOMO = bebio tomo trago comio bebido tomado tragado agarro agarrado comido chupo cogio metio uso
MEDMIA = medicina jarabe budesonida ampolla ampollas mezcla inhalador dosis medicamento mi_vaso puffs corticoide
DOBLE = dos_veces doble_dosis dosis_doble dos_dosis doble otra_dosis dosis_de_mas tomar_de_mas duplique
    repeti_la_dosis tres_dosis demasiada demasiado_medicamento dos_ampollas_de_mas
DIARIO = al_dia diarias cada_dia por_dia diario
VIRUELA = varicela sarampion viruela
CIRUGIA = cirugia operar operan operacion anestesia quirofano
"""
